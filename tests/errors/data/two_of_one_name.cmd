cat > jobs/two.json <<'END'
{ "recipe": "topup", "given": { "melt": "31.2 g", "melt_fineness": "752 ‰", "needed": "34 g", "promised": "750 ‰", "jars": [
  { "name": "585", "fineness": "14K" },
  { "name": "750", "fineness": "18K" },
  { "name": "585 ", "fineness": "999.9 ‰" } ] },
  "house": { "scale_step": "0.01 g" } }
END
lemel run jobs/two.json
