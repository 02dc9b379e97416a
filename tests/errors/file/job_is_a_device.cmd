lemel run /dev/zero
