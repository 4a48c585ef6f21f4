#!/bin/sh
# Build the wheel, install it with its locked requirements only, and use it from another folder.
set -eu
cd "$(dirname "$0")/.."
root=$PWD
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
cp -R pyproject.toml README.md LICENSE src "$room/"
(cd "$room" && "$root/.venv/bin/python" -m hatchling build -t wheel -d "$room/dist" >/dev/null)
"${PYTHON:-python3}" -m venv "$room/venv"
"$root/.venv/bin/uv" pip install --quiet --python "$room/venv/bin/python" --require-hashes -r requirements.lock
"$root/.venv/bin/uv" pip install --quiet --python "$room/venv/bin/python" --no-deps "$room"/dist/*.whl
cd "$room"
rm -rf src
"$room/venv/bin/wickwright" fit WH-302 renew-chimney --lost chimney --at 1700m --json >answer.json
"$room/venv/bin/python" - <<'PY'
import json
answer = json.load(open("answer.json"))
best = answer["routes"][0]
print("from the installed wheel:", best["price"], [part["part"] for part in best["buy"]])
PY
