#!/bin/sh
# Chromium for the browser's tests, and certutil, with which one of them has it trust a certificate:
# those that are here, or else from the system's packages.
set -eu

browser=""
for name in chromium chromium-browser google-chrome google-chrome-stable; do
  if command -v "$name" >/dev/null 2>&1; then
    browser=here
  fi
done
if [ -n "$browser" ] && command -v certutil >/dev/null 2>&1; then
  exit 0
fi

as_root=""
if [ "$(id -u)" -ne 0 ]; then
  if command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
    as_root="sudo -n"
  else
    echo "The browser's tests need Chromium and certutil. Install them (Debian: apt install chromium libnss3-tools), then try again." >&2
    exit 1
  fi
fi

# a browser that is here under any of its names is not installed once more
install() {
  if [ -n "$browser" ]; then echo "$2"; else echo "$1 $2"; fi
}

echo "Installing Chromium and certutil from the system's packages, where they are missing."
if command -v apt-get >/dev/null 2>&1; then
  export DEBIAN_FRONTEND=noninteractive
  wanted=$(install chromium libnss3-tools)
  # shellcheck disable=SC2086 - one or two packages
  if ! $as_root apt-get install -y -qq --no-install-recommends $wanted >/dev/null 2>&1; then
    $as_root apt-get update -qq
    $as_root apt-get install -y -qq --no-install-recommends $wanted >/dev/null
  fi
elif command -v dnf >/dev/null 2>&1; then
  $as_root dnf install -y -q $(install chromium nss-tools)
elif command -v pacman >/dev/null 2>&1; then
  $as_root pacman -S --noconfirm --quiet $(install chromium nss)
else
  echo "The browser's tests need Chromium and certutil, and no package manager is known here. Install them, then try again." >&2
  exit 1
fi
