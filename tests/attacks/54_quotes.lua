-- want: OK
return { out = "\"}]}, \"stopped\": false" }
