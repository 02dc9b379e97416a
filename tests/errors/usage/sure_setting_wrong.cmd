lemel sure jobs/links.json charge share=5
