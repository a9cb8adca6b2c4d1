#!/bin/sh
# In a repository of its own: does git diff name the block of a rig file that a change is in?
# The setting is the one that README.md gives, the attribute the one of this repository.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

setting=$(sed -n "s/^git config --global diff\.rig\.xfuncname '\(.*\)'$/\1/p" "$here/README.md")
[ -n "$setting" ] || { echo "not ok - README.md gives no setting"; exit 1; }

cd "$work"
git init -q .
git config user.name Tester
git config user.email tester@example.invalid
git config diff.rig.xfuncname "$setting"
cp "$here/../../.gitattributes" .

cat > tour.rig <<'RIG'
gear Quernock {
  in  midi : midi on din-5
  part voice receives midi on channel any
  clock follows internal, midi
  // 1
  // 2
  // 3
}

device bass : Quernock at (0.4 m, 1 m) {
  // 1
  // 2
  // 3
  // 4
  voice on channel 2
}

device left : Speaker {
// typed in a hurry: nothing is indented
thru off
gain 3 dB
clock midi
}

// ---- Cables ----

connect a.out to b.in
connect c.out to d.in
connect e.out to f.in
RIG
git add .
git commit -q -m "before"
sed -i.old 's/channel 2/channel 3/; s|  // 2|  // two|; s/clock midi$/clock internal/; s/f\.in/g.in/' tour.rig

failures=0
names() {
  if git diff -U0 tour.rig | grep -q "^@@ .* @@ $1"; then echo "ok - git diff names $1"; else
    echo "not ok - git diff does not name $1:"
    git diff -U0 tour.rig
    failures=1
  fi
}
names "gear Quernock {"
names "device bass : Quernock at (0.4 m, 1 m) {"
names "device left : Speaker {"
names "// ---- Cables ----"
exit "$failures"
