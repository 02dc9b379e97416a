lemel run charge lots='[]' mass='40 g' scale_step='0.01 g' target=0.585
