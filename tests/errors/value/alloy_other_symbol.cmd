# Palladium is no slip in silver; in whatever case it is typed.
for metal in 'Pd999 fine' 'pd999' 'Ag925 sterlin'; do lemel run need metal="$metal" wax="2 g"; done
