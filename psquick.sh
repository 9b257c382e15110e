#!/usr/bin/env bash
set -e -o pipefail
cd /work/wt/partscreen; export PYTHONPATH=$PWD
for try in 1 2 3; do
  git rebase -q main
  timeout 200 /work/main/.venv/bin/python -m pytest -q -x tests/tui/test_part_job.py tests/tui/test_part_door.py "$@" 2>&1 | tail -3
  git -C /work/main merge --ff-only partscreen 2>&1 | tail -1 && exit 0 || true
done
