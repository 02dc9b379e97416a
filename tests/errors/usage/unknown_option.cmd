lemel run --hose x
