"""What a document says of itself as XMP: title, author, subject, and that it is made to PDF/UA-1.

ISO 14289-1 (PDF/UA-1), clauses 5 and 7.1, and ISO 16684-1 (XMP), recalled.
"""

from __future__ import annotations

from typing import Any
from xml.sax.saxutils import escape

_MARK = '<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>'
_PACKET = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt></dc:description>
</rdf:Description>
{mark}
</rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>"""


def metadata(info: Any, is_accessible: bool) -> bytes:
    """The XMP packet of the properties `info`. It names PDF/UA only where the document `is_accessible` as far as is
    known: not where a page of others is bound in whose letters cannot be read out. No clock is read."""
    said = {name: escape(str(getattr(info, name) or "")) for name in ("title", "author", "subject")}
    return _PACKET.format(**said, mark=_MARK if is_accessible else "").encode()
