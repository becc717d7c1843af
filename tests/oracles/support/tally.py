"""What an oracle found: how many checks passed and failed."""

passed = failed = 0


def check(what, holds, *numbers):
    """Counts a check, tells of one that fails, and says whether it holds."""
    global passed, failed
    if holds:
        passed += 1
    else:
        failed += 1
        print(f"FAILED: {what}", *numbers)
    return bool(holds)


def near(what, found, expected, tolerance):
    """Counts a check that two numbers are no further apart than the tolerance."""
    return check(what, abs(found - expected) <= tolerance, found, expected, abs(found - expected))


def close():
    """Prints the line that is counted; gives the exit code."""
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0
