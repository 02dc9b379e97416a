cat > j.json <<'END'
{ "recipe": "pour",
  "given": { "wax": "2 g" } }
END
lemel run j.json
