cat > j.json <<'END'
{ "recipe": "cast",
  "given": {
END
lemel run j.json
