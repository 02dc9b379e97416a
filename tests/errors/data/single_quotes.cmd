cat > j.json <<'END'
{ 'recipe': 'cast' }
END
lemel run j.json
