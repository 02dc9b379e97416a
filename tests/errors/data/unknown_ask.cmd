cat > j.json <<'END'
{ "recipe": "cast",
  "given": { "wacks": "2 g", "density": "15 g/cm3" } }
END
lemel run j.json
