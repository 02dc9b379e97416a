cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel what jobs/cuff-links.json price by "old_metal[9].gross"="10..20 g"
