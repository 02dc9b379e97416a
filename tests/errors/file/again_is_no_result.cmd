# No line of another file is shown, whatever it is.
printf 'root:secret:0:0\n' > passwords
lemel again passwords
