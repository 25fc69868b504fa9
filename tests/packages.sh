# SPDX-License-Identifier: GPL-3.0-or-later
# The Debian packages that Tankwright needs, and the way to get them; read by tests/run and samples/try.
# shellcheck shell=sh

# To build and use the program. librsvg2-common: without it our own symbols show as missing pictures;
# desktop-file-utils: the build registers the media type with it.
build_packages='gcc libc6-dev meson ninja-build pkg-config gettext libgtk-4-dev libadwaita-1-dev libcjson-dev
  libgeos-dev libgsl-dev libcairo2-dev libpango1.0-dev desktop-file-utils librsvg2-common adwaita-icon-theme
  shared-mime-info'

# To test it: a virtual display with input and accessibility, fonts that are always the same, second opinions on
# what the program writes (and a second polygon library), a second compiler, the tools of the house rules.
test_packages='xvfb dbus-daemon at-spi2-core xdotool libxtst-dev python3-gi python3-jsonschema gir1.2-atspi-2.0 fonts-cantarell
  fonts-dejavu-core poppler-utils qpdf appstream libxml2-utils locales imagemagick clang libclang-rt-14-dev
  clang-format-14 groff-base g++ libpolyclipping-dev'

# missing_packages NAME...: prints those that are not installed, each after a space.
missing_packages() {
  for package in "$@"; do
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || state=none
    [ "$state" = installed ] || printf ' %s' "$package"
  done
}

# install_packages AGAIN NAME...: installs what is missing of NAME... without asking, or says which command
# does it and ends the script. AGAIN is the command to repeat afterwards.
install_packages() {
  again=$1
  shift
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "This is not Debian or a relative, so nothing is installed here. What is needed is in these packages:"
    echo "  $*" | tr -s '\n ' ' '
    echo
    return 0
  fi
  missing=$(missing_packages "$@")
  [ -n "$missing" ] || return 0

  if [ "$(id -u)" = 0 ]; then
    as_root=
  elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
    as_root='sudo -n'
  else
    {
      echo "Not installed:$missing"
      echo "I may not install packages here. Have this run by someone who may, then repeat: $again"
      echo "  sudo apt-get update && sudo apt-get install -y --no-install-recommends$missing"
    } >&2
    exit 1
  fi

  echo "Installing:$missing"
  apt_log=$(mktemp)
  # shellcheck disable=SC2086
  if $as_root apt-get -q -o DPkg::Lock::Timeout=300 update </dev/null >"$apt_log" 2>&1 &&
     $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300 install \
       --no-install-recommends $missing </dev/null >>"$apt_log" 2>&1; then
    rm -f "$apt_log"
    return 0
  fi
  {
    tail -n 20 "$apt_log"
    rm -f "$apt_log"
    echo "The packages could not be installed (above: what apt-get said last). Put that right, then repeat: $again"
    echo "  apt-get update && apt-get install -y --no-install-recommends$missing"
  } >&2
  exit 1
}
