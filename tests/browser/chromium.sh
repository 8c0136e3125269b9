#!/bin/sh
# Chromium for the browser's tests: the one that is here, or else from the system's packages.
set -eu

for name in chromium chromium-browser google-chrome google-chrome-stable; do
  if command -v "$name" >/dev/null 2>&1; then
    exit 0
  fi
done

as_root=""
if [ "$(id -u)" -ne 0 ]; then
  if command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
    as_root="sudo -n"
  else
    echo "The browser's tests need Chromium. Install it (Debian: apt install chromium), then try again." >&2
    exit 1
  fi
fi

echo "Installing Chromium from the system's packages, once."
if command -v apt-get >/dev/null 2>&1; then
  export DEBIAN_FRONTEND=noninteractive
  if ! $as_root apt-get install -y -qq --no-install-recommends chromium >/dev/null 2>&1; then
    $as_root apt-get update -qq
    $as_root apt-get install -y -qq --no-install-recommends chromium >/dev/null
  fi
elif command -v dnf >/dev/null 2>&1; then
  $as_root dnf install -y -q chromium
elif command -v pacman >/dev/null 2>&1; then
  $as_root pacman -S --noconfirm --quiet chromium
else
  echo "The browser's tests need Chromium, and no package manager is known here. Install it, then try again." >&2
  exit 1
fi
