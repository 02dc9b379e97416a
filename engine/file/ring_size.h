/* Ring size: how one is written, "US 6 1/4", "UK L 1/2", "UK Z+1", "ISO 52.5", "JP 12", "CH 12.5".
 *
 * The form alone: what a size is in millimetres, and how far its chart goes, is in
 * scripts/ring_sizes.lua. Without its system, a size is of the one that the house's country uses: a
 * letter in Australia, a number in Japan.
 *
 *     char size[LML_RING_SIZE_TEXT];
 *     lml_ring_size_read(lml_span_of("L 1/2"), house, size);       "AU L 1/2"
 */
#ifndef LML_FILE_RING_SIZE_H
#define LML_FILE_RING_SIZE_H

#include "file/json.h"

enum { LML_RING_SIZE_TEXT = 48 };

/* With its system. `house` may be NULL. */
bool lml_ring_size_read(lml_span text, const lml_json *house, char out[LML_RING_SIZE_TEXT]);
/* As it is written where the house is, without the system; NULL where its country is not known. */
const char *lml_ring_size_example(const lml_json *house);

#endif
