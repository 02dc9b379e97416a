cat > j.json <<'END'
{ "recipe": "pour", "given": { "wax": "2 g", "density": "15 g/cm3" },
  "house": { "pour.crucibel": "1 cm3" } }
END
lemel run j.json
