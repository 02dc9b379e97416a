cat > j.json <<'END'
{ "recipe": "cast",
  "recipe": "cast" }
END
lemel run j.json
