#!/usr/bin/env bash
# Installs what the tests need, runs everything, ends with "N passed, N failed, N skipped".
set -uo pipefail
cd "$(dirname "$0")/.."

missing=()
command -v chromium >/dev/null || missing+=(chromium)
command -v mosquitto >/dev/null || [ -x /usr/sbin/mosquitto ] || missing+=(mosquitto)
command -v socat >/dev/null || missing+=(socat)
command -v openssl >/dev/null || missing+=(openssl)
command -v python3 >/dev/null || missing+=(python3)
if [ ${#missing[@]} -gt 0 ] && command -v apt-get >/dev/null; then
  sudo=''; [ "$(id -u)" = 0 ] || sudo='sudo'
  $sudo apt-get update -q && DEBIAN_FRONTEND=noninteractive $sudo apt-get install -qy --no-install-recommends "${missing[@]}" || exit 1
fi

if [ ! -e node_modules/.package-lock.json ] || [ package-lock.json -nt node_modules/.package-lock.json ]; then
  npm ci --no-audit --no-fund || exit 1
fi

failed=0
step() { printf '\n== %s\n' "$1"; shift; "$@" || failed=1; }
step 'formatting' npm run --silent format:check
step 'types' npm run --silent types
step 'lint' npm run --silent lint
step 'build' npm run --silent build

report=$(mktemp -d)
trap 'rm -rf "$report"' EXIT
printf '\n== tests\n'
npx --no vitest run --reporter=default --reporter=json --outputFile.json="$report/tests.json" || failed=1
node -e '
  const { readFileSync } = require("node:fs")
  let r = { numPassedTests: 0, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0, success: false }
  try { r = JSON.parse(readFileSync(process.argv[1], "utf8")) } catch {}
  const bad = process.argv[2] === "1" && r.numFailedTests === 0 ? 1 : 0
  console.log(`\n${r.numPassedTests} passed, ${r.numFailedTests + bad} failed, ${r.numPendingTests + r.numTodoTests} skipped`)
' "$report/tests.json" "$failed"
exit "$failed"
