-- want: BAD_RECIPE "text cannot be changed"
text.fill = nil
