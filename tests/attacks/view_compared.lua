-- want: OK
return { out = job == house or sheet == job }
