cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel what jobs/cuff-links.json stamp by markup="10..30 %"
