# A result that a stranger made names any file as its job.
echo 'root:secret:0:0' > passwords
lemel run jobs/links.json -q --format json 2>/dev/null | sed 's|jobs/links.json|passwords|' > r.json
lemel again r.json
