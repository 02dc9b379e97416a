cat > j.json <<'END'
{ "recipe": "pour", "givn": {} }
END
lemel run j.json
