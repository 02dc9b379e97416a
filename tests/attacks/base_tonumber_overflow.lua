-- want: OK
return { out = tonumber("1e999") == nil and tonumber("0x10") == nil and tonumber("nan") == nil and tonumber("inf") == nil }
