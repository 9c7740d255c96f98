import { defineConfig } from 'vite'

/** The page: built from `web/` into `dist/web`, served by the server from there. */
export default defineConfig({
  root: 'web',
  base: '/',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: { outDir: '../dist/web', emptyOutDir: true, target: 'es2023', sourcemap: false },
})
