cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel why jobs/cuff-links.json "weigh[99].mass"
