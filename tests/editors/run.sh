#!/usr/bin/env bash
# Tries everything that editors get: grammars and settings under Node, the VS Code package, the protocol's schema, and two real
# editors against the server. RIG names the rig program; without it, the debug build is taken, and made if it is not there.
# Ends with a line "N passed, N failed"; fails when anything failed or nothing ran.
set -u
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
passed=0
failed=0
log=$(mktemp)
trap 'rm -f "$log"' EXIT

step() {
  local name=$1
  shift
  if "$@" >"$log" 2>&1; then
    echo "ok - $name"
    passed=$((passed + 1))
  else
    cat "$log"
    echo "not ok - $name"
    failed=$((failed + 1))
  fi
}

# The lines "ok" and "not ok" that a command prints; one that dies without a word counts as failed.
tests() {
  local name=$1 status
  shift
  timeout 300 "$@" >"$log" 2>&1
  status=$?
  grep -aE '^(ok|not ok)|^  ' "$log" | grep -avE '^  (---|\.\.\.|duration_ms|type:)'
  local good bad
  good=$(grep -acE '^ok' "$log")
  bad=$(grep -acE '^not ok' "$log")
  if [ "$bad" -eq 0 ] && { [ "$status" -ne 0 ] || [ "$good" -eq 0 ]; }; then
    tail -n 20 "$log"
    echo "not ok - $name ended with $status after $good tests"
    bad=1
  fi
  passed=$((passed + good))
  failed=$((failed + bad))
}

needed=()
command -v nvim >/dev/null || needed+=(neovim)
command -v emacs >/dev/null || needed+=(emacs-nox)
[ -d /usr/share/emacs/site-lisp/elpa ] && ls /usr/share/emacs/site-lisp/elpa | grep -q '^eglot' || needed+=(elpa-eglot)
command -v git >/dev/null || needed+=(git)
if [ ${#needed[@]} -gt 0 ]; then
  step "Debian packages: ${needed[*]}" sh -c "apt-get update -qq && apt-get install -y -qq --no-install-recommends ${needed[*]}"
fi

in_folder() { (cd "$1" && shift && "$@"); }
quiet=(--no-audit --no-fund)
step "protocol-schema: npm ci" in_folder "$root/tests/protocol-schema" npm ci "${quiet[@]}"
step "protocol-schema: the schema is what the typings give" in_folder "$root/tests/protocol-schema" npm run -s check
step "vscode: npm ci" in_folder "$root/editors/vscode" npm ci "${quiet[@]}"
step "vscode: types, bundle and package" in_folder "$root/editors/vscode" npm run -s package
step "editors: npm ci" in_folder "$here" npm ci "${quiet[@]}"
cd "$here" || exit 1
tests "node" node --test --test-reporter=tap

RIG=${RIG:-$root/src/RigLang.Cli/bin/Debug/net10.0/rig}
[ -x "$RIG" ] || step "the rig program" dotnet build "$root/src/RigLang.Cli"
export RIG EDITORS="$root/editors"

# Each editor gets a copy of the examples of its own to change, and none of the user's settings.
editor() {
  local name=$1 copy
  shift
  copy=$(mktemp -d)
  cp -r "$root/examples" "$copy"
  # A rig imports from its repository, so the copy is one.
  git init -q "$copy"
  tests "$name" env EXAMPLES="$copy/examples" HOME="$copy" XDG_CONFIG_HOME="$copy" XDG_DATA_HOME="$copy" XDG_CACHE_HOME="$copy" "$@"
  rm -rf "$copy"
}
editor nvim nvim --headless -u NONE -i NONE -c "luafile $here/nvim/test.lua"
editor emacs emacs --batch -l "$here/emacs/test.el"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
