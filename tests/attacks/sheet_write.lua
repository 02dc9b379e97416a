-- want: BAD_RECIPE "written by its own functions only"
sheet.bench = nil
