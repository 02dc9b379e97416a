lemel units ozz
