-- want: OK
return { out = ("\xff\xfe"):upper() }
