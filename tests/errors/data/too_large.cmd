cat > j.json <<'END'
{ "recipe": "cast",
  "given": { "wax": "3 kg", "density": "15 g/cm3" } }
END
lemel run j.json
