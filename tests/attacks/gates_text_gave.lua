-- want: OK "\"stopped\":true"
return { poured = "99 kg" }
