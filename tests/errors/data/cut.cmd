cat > j.json <<'END'
{ "recipe": "pour",
  "given": {
END
lemel run j.json
