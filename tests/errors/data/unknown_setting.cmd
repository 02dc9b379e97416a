cat > j.json <<'END'
{ "recipe": "cast", "given": { "wax": "2 g", "density": "15 g/cm3" },
  "house": { "cast.crucibel": "1 cm3" } }
END
lemel run j.json
