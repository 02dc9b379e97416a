-- want: MISMATCH "cannot be added"
-- One piece came in today: the sum of its temperature is no more a sum than that of two.
return { out = sum { Q "20 °C" } }
