mkdir elsewhere && ln -s elsewhere .lemel
lemel new annotations --replace; status=$?
ls elsewhere >&2
exit $status
