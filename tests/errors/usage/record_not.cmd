# What was recorded and never done is taken back, where it is in the record and was not weighed.
lemel record jobs/links.json "not poured"
lemel record jobs/links.json "raw casting" "31.02 g" note="dry" --at 2026-11-26T14:20 -q
lemel record jobs/links.json "not raw casting"
lemel record jobs/links.json poured --at 2026-11-26T14:00 --anyway -q
lemel record jobs/links.json "not poured" --at 2026-11-26T13:59
# Of two that stand the later one counts: what takes the earlier one back alone would change nothing.
lemel record jobs/links.json poured --at 2026-11-26T15:00 --anyway -q
lemel record jobs/links.json "not poured" --at 2026-11-26T14:30
lemel record jobs/links.json "not poured" --at 2026-11-26T14:30 --anyway -q
lemel record jobs/links.json "not poured" --at 2026-11-26T14:45 --anyway
lemel record jobs/links.json "not poured" --at 2026-11-26T15:00 -q
