lemel run charge mass="10 g" target="585 ‰ Au" scale_step="0.01 g" lots='[{"name": "old button", "metal": "587 ‰ Au", "from": "red-ring: button"}]' --sheet bench -q | grep -A4 STOP >&2
