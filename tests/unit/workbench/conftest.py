"""The small class as a document, for tests of the open class."""

import pytest

from jarwright.model.document import ClassDocument, document_from_json


@pytest.fixture
def document(small_class) -> ClassDocument:
    """Return the small class."""
    return document_from_json(small_class)
