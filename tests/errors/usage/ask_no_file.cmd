lemel ask cast
