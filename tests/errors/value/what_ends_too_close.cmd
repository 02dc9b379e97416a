for range in "0..1e-323 g" "1..1.0000000000000002 g" "1e999..2e999 g" "0..1e308 g"; do lemel what jobs/links.json charge by wax="$range"; done
