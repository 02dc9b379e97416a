# The body is sure enough, but not a part of the same metal: a finer body does not help.
lemel run mark mark=14K destination=US date=2026-11-24 body='9.90 g' body_fineness='590 ‰ Au ± 1 ‰' parts='[{"what": "T-bars", "mass": "2.30 g", "fineness": "581 ‰ ± 3 ‰"}]' --format json -q >/dev/null
