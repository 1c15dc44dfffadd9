#!/bin/sh
# Sees to it that the browsers which the journey tests drive are here:
# Chromium, the tool that puts a certificate into its store, WPE WebKit and a
# font; and the C compiler that the race detector needs. Root gets them from Debian; anyone else is told what is missing.
# Silent, and quick, when everything is here.
set -eu

missing=
need() { # need PACKAGE COMMAND-OR-FILE
	command -v "$2" >/dev/null 2>&1 || [ -f "$2" ] || missing="$missing $1"
}
need chromium chromium
need libnss3-tools certutil
need wpewebkit-driver WPEWebDriver
need cog cog
need gcc gcc
need libc6-dev /usr/include/stdio.h
[ -n "$(find /usr/share/fonts /usr/local/share/fonts -name '*.ttf' -print -quit 2>/dev/null)" ] || missing="$missing fonts-dejavu-core"
[ -n "$missing" ] || exit 0

# missing is a list of words on purpose, here and below.
if [ "$(id -u)" -ne 0 ] || ! command -v apt-get >/dev/null 2>&1; then
	{
		echo "The tests drive real browsers, and these Debian packages are not installed:$missing"
		echo "Install them with:"
		echo "    sudo apt-get update && sudo apt-get install --no-install-recommends$missing"
	} >&2
	exit 1
fi

echo "Installing$missing" >&2
log=$(mktemp)
trap 'rm -f "$log"' EXIT
export DEBIAN_FRONTEND=noninteractive
# shellcheck disable=SC2086
if ! { apt-get -q update && apt-get -qy install --no-install-recommends $missing; } >"$log" 2>&1; then
	tail -n 30 "$log" >&2
	echo "Installing$missing failed; the end of what apt-get said stands above." >&2
	exit 1
fi
