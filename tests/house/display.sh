#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The wrapper of the window tests: a display, a bus, the command's own exit status, nothing left behind.
cd "$(dirname "$0")/.." || exit 1
TMPDIR=$(mktemp -d) || exit 1
export TMPDIR
trap 'rm -rf "$TMPDIR"' EXIT
command -v xdotool >/dev/null || { echo "1..0 # SKIP xdotool is not installed"; exit 0; }

number=0
ok() {
  number=$((number + 1))
  if [ "$1" = "$2" ]; then echo "ok $number - $3"; else echo "not ok $number - $3"; echo "# $1 is not $2"; fi
}

ok "$(TW_SCREEN=900x700x24 sh with-display.sh xdotool getdisplaygeometry)" "900 700" "a screen of the size asked for"
# shellcheck disable=SC2016
ok "$(sh with-display.sh sh -c 'echo "${DBUS_SESSION_BUS_ADDRESS%%:*} $GSETTINGS_BACKEND"')" "unix memory" "a bus, settings in memory"
ok "$(echo typed | sh with-display.sh cat)" typed "standard input goes to the command"
sh with-display.sh sh -c 'exit 3'
ok $? 3 "exit status of the command"
sh with-display.sh sh -c 'kill -TERM $PPID; exec sleep 20'
ok $? 143 "a signal ends it at once"
ok "$(find "$TMPDIR" -mindepth 1 | wc -l)" 0 "nothing is left behind"
echo "1..$number"
