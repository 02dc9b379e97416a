cat > j.json <<'END'
{ "recipe": "pour",
  "recipe": "pour" }
END
lemel run j.json
