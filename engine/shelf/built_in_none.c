/* No text is built in: for the program that the build makes the rows with, and for a build that
 * does without them. */
#include "shelf/built_in.h"

const lml_built_in lml_built_in_rows[1] = {{.name = "", .text = ""}};
const char lml_built_in_words[1] = "";
const lml_built_in_shape lml_built_in_shapes[1] = {{.name = 0}};
const uint32_t lml_built_in_names[1] = {0};
const size_t lml_built_in_count = 0, lml_built_in_scripts = 0;
const char *const lml_built_in_lua = "";
