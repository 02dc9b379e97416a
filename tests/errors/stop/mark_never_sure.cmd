# 999 is asked of metal that is known to half a thousandth: no metal is that fine.
lemel run mark mark=999 destination=UK date=2026-11-24 body='9.90 g' body_fineness='999.2 ‰ Au ± 0.7 ‰' --format json -q >/dev/null
