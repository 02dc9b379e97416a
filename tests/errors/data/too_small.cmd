cat > j.json <<'END'
{ "recipe": "cast",
  "given": { "wax": "0.01 g", "density": "15 g/cm3" } }
END
lemel run j.json
