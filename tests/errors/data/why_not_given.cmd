cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel why jobs/cuff-links.json price "old_metal[0].gross"="1 g"
