import { type Plugin, type Rolldown, defineConfig } from 'vite'

/** The page: built from `web/` into `dist/web`, served by the server from there. */
export default defineConfig({
  root: 'web',
  base: '/',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [programAtOnce()],
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2023',
    sourcemap: false,
    modulePreload: { polyfill: false },
  },
})

/** `begin.ts` imports the program; the document names it and what it is made of, so that all is fetched together. */
function programAtOnce(): Plugin {
  return {
    name: 'program-at-once',
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { bundle = {} }) =>
        Object.values(bundle)
          .filter((file) => file.type === 'chunk')
          .filter(({ facadeModuleId }) => facadeModuleId?.endsWith('/web/main.tsx') === true)
          .flatMap(({ fileName, imports }) =>
            [fileName].concat(imports.filter((name) => !isEntry(bundle, name))),
          )
          .map((name) => ({
            tag: 'link',
            injectTo: 'head' as const,
            attrs: { rel: 'modulepreload', href: `/${name}` },
          })),
    },
  }
}

function isEntry(
  bundle: Readonly<Record<string, Rolldown.OutputChunk | Rolldown.OutputAsset>>,
  name: string,
): boolean {
  const file = bundle[name]
  return file?.type === 'chunk' && file.isEntry
}
