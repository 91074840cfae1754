# Shared by .ci/open and .ci/run: a virtual environment in .venv, filled only when something it needs has changed.

say() { printf '%s\n' "$*" >&2; }

find_python() { # the first Python of 3.11 or later; prints nothing when there is none
  local name
  for name in python3 python3.14 python3.13 python3.12 python3.11 python; do
    if command -v "$name" >/dev/null && "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
      printf '%s\n' "$name"
      return
    fi
  done
}

make_venv() { # make_venv REQUIREMENTS_FILE...
  local python wanted stamp=.venv/installed options=() file
  wanted=$(pwd; cat linelib/pyproject.toml "$@" | cksum)
  if [ -x .venv/bin/python ] && [ "$(cat "$stamp-$#" 2>/dev/null)" = "$wanted" ]; then return 0; fi
  if ! .venv/bin/python -m pip --version >/dev/null 2>&1; then
    python=$(find_python)
    if [ -z "$python" ]; then
      say "Python 3.11 or later is needed; found: $(python3 --version 2>/dev/null || echo none)."
      return 1
    fi
    if ! "$python" -m venv --clear .venv; then
      say "$python cannot make a virtual environment. On Debian or Ubuntu: apt-get install python3-venv"
      return 1
    fi
  fi
  for file in "$@"; do options+=(-r "$file"); done
  say "Installing into .venv (once; this takes a few minutes) ..."
  if ! .venv/bin/python -m pip install --quiet --disable-pip-version-check "${options[@]}"; then
    say "pip could not install what ${*} asks for; see its message above."
    return 1
  fi
  printf '%s\n' "$wanted" >"$stamp-$#"
}
