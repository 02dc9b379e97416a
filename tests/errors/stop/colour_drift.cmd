# Too little copper went in: the red ring comes out yellow.
. "$(dirname "$0")/remake.sh"
sed "s/\"notes\"/\"record\": [ $(weighed 0 bangle '14.400 g'), $(weighed 1 'fine gold' '5.665 g'), $(weighed 2 copper '0.500 g') ], \"notes\"/" \
    "$examples/jobs/red-ring.json" >jobs/red.json
asks colour-drift jobs/red.json
