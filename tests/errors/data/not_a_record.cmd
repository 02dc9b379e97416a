cat > j.json <<'END'
[1]
END
lemel run j.json
