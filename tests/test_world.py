"""The process is left as it was found."""

import gc

import pytest

from pantry.world import without_collecting


def test_garbage_is_looked_for_again_after_work_that_had_none_looked_for_even_where_it_failed():
    with without_collecting():
        with without_collecting():
            assert not gc.isenabled()
        assert not gc.isenabled()
    assert gc.isenabled()
    with pytest.raises(ZeroDivisionError), without_collecting():
        raise ZeroDivisionError
    assert gc.isenabled()


def test_what_did_not_look_for_garbage_before_does_not_afterwards():
    gc.disable()
    try:
        with without_collecting():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
