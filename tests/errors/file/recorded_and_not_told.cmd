lemel record jobs/links.json tree mass="31 g" --at 2026-11-26T14:20 >/dev/full
