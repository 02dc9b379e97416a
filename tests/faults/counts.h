/* Counts: what the allocator that fails and the program that started it tell each other, in a
 * mapped file. */
#ifndef LML_TESTS_FAULTS_COUNTS_H
#define LML_TESTS_FAULTS_COUNTS_H

#include <stdint.h>

enum { FAULT_PROCESSES = 16 };

struct fault_counts {
    int64_t fail_process, fail_call; /* the call counts from 1; 0 fails none */
    int64_t reached;
    int64_t processes, calls[FAULT_PROCESSES];
};

#endif
