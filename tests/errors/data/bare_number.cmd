cat > j.json <<'END'
{ "recipe": "cast",
  "given": { "wax": 2, "density": "15 g/cm3" } }
END
lemel run j.json
