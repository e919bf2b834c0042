# Files of papers (api/papers.py).

api-papers-no-pdf = This is not a PDF. Save it as PDF again, then send that.
api-papers-no-png = This is not a whole PNG picture. Save it as PNG or JPEG again.
api-papers-no-base64 = The file is not Base64 (RFC 4648). Export it again.
