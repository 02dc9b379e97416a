cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel sure jobs/cuff-links.json Mark
