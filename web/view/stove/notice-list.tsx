import { usePage, useWords } from '../page-context.ts'
import { noticeTold } from '../words/told-text.ts'

/** What the watch told lately, newest first; also what was missed while this page was away. */
export function NoticeList({ potId }: { readonly potId?: string }) {
  const { w, f } = useWords()
  const { notices: all, pots, isMoreInRecord } = usePage().state.stove.value
  const notices = all.filter((n) => potId === undefined || n.pot === potId).slice(0, 12)
  if (notices.length === 0) return null
  return (
    <section class="notices">
      <h2>{w.stove.notices}</h2>
      <ul>
        {notices.map((notice) => (
          <li key={notice.id}>
            <time dateTime={notice.at}>{f.clock(Date.parse(notice.at))}</time>{' '}
            {noticeTold(notice, pots ?? [], f)}
          </li>
        ))}
      </ul>
      {isMoreInRecord && <p class="hint">{w.stove.moreInRecord}</p>}
    </section>
  )
}
