# Fine gold that is known to half a thousandth, for a mark of 999.5.
lemel run charge mass='20 g' target='999.6 ‰ Au' promised='999.5 ‰ Au' scale_step='0.01 g' lots='[{"name": "fine gold", "metal": "999.6 ‰ Au ± 0.5 ‰"}]' --format json -q >/dev/null
