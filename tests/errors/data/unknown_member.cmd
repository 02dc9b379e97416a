cat > j.json <<'END'
{ "recipe": "cast", "givn": {} }
END
lemel run j.json
