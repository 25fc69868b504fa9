#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# with-display.sh COMMAND...: runs COMMAND on an X server, a session bus and a home of its own, and removes all
# three afterwards. Where they are not installed the TAP line says "skipped"; with CI=true that is a failure.
set -u
[ $# -gt 0 ] || { echo "usage: $0 COMMAND..." >&2; exit 2; }
for program in Xvfb dbus-daemon; do
  command -v $program >/dev/null && continue
  [ "${CI-}" = true ] && { echo "$program is not installed" >&2; exit 1; }
  echo "1..0 # SKIP $program is not installed"
  exit 0
done

dir=$(mktemp -d -t tw-display.XXXXXX) || exit 1
pids=
finish() {
  for p in $pids; do kill "$p" 2>/dev/null; done   # newest first: program, bus, X server
  for p in $pids; do wait "$p" 2>/dev/null; done
  rm -rf "$dir"
}
trap 'rc=$?; trap - EXIT; finish; exit $rc' EXIT
trap 'exit 129' HUP
trap 'exit 130' INT
trap 'exit 143' TERM
mkdir -m 700 "$dir/run" "$dir/home"
mkfifo "$dir/x" "$dir/bus"   # a pipe each: on a shared one the two answers race

Xvfb -displayfd 3 -screen 0 "${TW_SCREEN:-1280x800x24}" -nolisten tcp -noreset 3>"$dir/x" >"$dir/xvfb.log" 2>&1 &
pids="$! $pids"
read -r display <"$dir/x" || { cat "$dir/xvfb.log" >&2; exit 1; }

unset WAYLAND_DISPLAY XAUTHORITY AT_SPI_BUS_ADDRESS GTK_THEME
export DISPLAY=":$display" GDK_BACKEND=x11 GSK_RENDERER="${GSK_RENDERER:-cairo}" HOME="$dir/home" \
  XDG_RUNTIME_DIR="$dir/run" XDG_CONFIG_HOME="$dir/home/.config" XDG_DATA_HOME="$dir/home/.local/share" \
  XDG_STATE_HOME="$dir/home/.local/state" XDG_CACHE_HOME="$dir/home/.cache" \
  GSETTINGS_BACKEND=memory ADW_DISABLE_PORTAL=1 GIO_USE_VFS=local \
  LC_ALL="${LC_ALL:-C.UTF-8}"

# The bus writes to a file: the accessibility registry inherits its stdout and would write into the test's TAP.
dbus-daemon --session --nofork --nopidfile --print-address=3 3>"$dir/bus" >"$dir/bus.log" 2>&1 &
pids="$! $pids"
read -r DBUS_SESSION_BUS_ADDRESS <"$dir/bus" || { cat "$dir/bus.log" >&2; exit 1; }
export DBUS_SESSION_BUS_ADDRESS

exec 4<&0
"$@" <&4 &   # in the background, so that a signal to this script acts at once
command=$!
pids="$command $pids"
wait "$command"
