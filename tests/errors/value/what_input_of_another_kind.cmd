cp -R "$(dirname "$(readlink -f "$(command -v lemel)")")"/share/lemel/examples/. .; lemel what jobs/cuff-links.json charge by button="1..60 USD"
