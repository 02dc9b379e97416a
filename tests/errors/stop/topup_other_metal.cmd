# Platinum out of a jar went into the gold.
lemel run topup melt='69.4 g' melt_fineness='780 ‰' needed='71 g' promised='750 ‰' scale_step='0.001 g' jars='[{"name": "old", "metal": "Pt950 cobalt", "mass": "20 g"}]' went_in='[{"jar": "old", "mass": "1.6 g"}]' --format json -q >/dev/null
