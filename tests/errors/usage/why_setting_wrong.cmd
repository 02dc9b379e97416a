lemel why jobs/links.json charge share=5
