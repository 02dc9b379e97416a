lemel confirm jobs/links.json cast/old share=5 --by O.F. --reason told
