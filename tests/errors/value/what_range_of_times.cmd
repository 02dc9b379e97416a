cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel what jobs/cuff-links.json start by pour="2026-11-27T12:00..2026-11-27T16:00"
