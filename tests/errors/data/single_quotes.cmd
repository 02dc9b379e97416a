cat > j.json <<'END'
{ 'recipe': 'pour' }
END
lemel run j.json
