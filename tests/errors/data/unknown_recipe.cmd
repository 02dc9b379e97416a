cat > j.json <<'END'
{ "recipe": "poor" }
END
lemel run j.json
