import { type Plugin, defineConfig } from 'vite'

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

/** `begin.ts` imports the program; the document names it too, so that both are fetched together. */
function programAtOnce(): Plugin {
  return {
    name: 'program-at-once',
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { bundle = {} }) =>
        Object.values(bundle).flatMap((file) =>
          file.type === 'chunk' && file.facadeModuleId?.endsWith('/web/main.tsx') === true
            ? [
                {
                  tag: 'link',
                  injectTo: 'head' as const,
                  attrs: { rel: 'modulepreload', href: `/${file.fileName}` },
                },
              ]
            : [],
        ),
    },
  }
}
