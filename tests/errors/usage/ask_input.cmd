lemel ask -
