# Counts what passed and failed in the log that ctest keeps (Testing/Temporary/LastTest.log). A program of
# Criterion says it in its synthesis, a script in its last line; a program that says neither counts as one,
# and one that failed without counting a failure (it crashed, it ran out of time) adds one.
/^[0-9]+\/[0-9]+ Testing: / { name = $3; passed = failed = 0 }
/Synthesis: Tested:/ {
    gsub(/[|:]/, " ")
    for (i = 1; i < NF; i++) {
        if ($i == "Passing") passed += $(i + 1)
        if ($i == "Failing" || $i == "Crashing") failed += $(i + 1)
    }
}
/[0-9]+ passed, [0-9]+ failed$/ { passed += $(NF - 3); failed += $(NF - 1) }
/^Test (Passed|Failed)\.$/ && name != "" {
    if ($2 == "Failed." && failed == 0) failed = 1
    if ($2 == "Passed." && passed == 0) passed = 1
    all_passed += passed
    all_failed += failed
    name = ""
}
END { print all_passed + 0, all_failed + 0 }
