cat > j.json <<'END'
{ "recipe": "pour", "given": { "wax": "2 g", "density": "15 g/cm3" },
  "confirmed": { "pour/old": { "by": "O.F." } } }
END
lemel run j.json
