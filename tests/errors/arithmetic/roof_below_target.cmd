# A roof that lies below what it roofs.
lemel run charge mass='10 g' target='585 ‰' roof='580 ‰' scale_step='0.01 g' lots='[{"name": "grain", "metal": "Au585 yellow"}]'
