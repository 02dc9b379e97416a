cat > j.json <<'END'
{ "recipe": "cast",
  "given": { "wax": "2 g" } }
END
lemel run j.json
