lemel run --quiet=yes
