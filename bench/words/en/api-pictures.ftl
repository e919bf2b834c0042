# Photographs of a batch (api/pictures.py).

api-pictures-title = The picture is wrong
api-pictures-send-jpeg = Send a JPEG as image/jpeg. A paper may be a PDF or PNG too: application/pdf, image/png.
api-pictures-no-entry = No entry tells of this picture. Send the entry first, then the picture.
api-pictures-another = The entry tells of another picture: its SHA-256 is another. Send that one.
api-pictures-broken = This is not a whole JPEG picture. Take it again, or save it as JPEG.
api-pictures-more-after = Something comes after the end of the picture. Save it again, as a picture alone.
api-pictures-more-beside = The picture holds more than itself, such as where and when it was taken. Save it without its data (Exif), then send that.
api-pictures-too-many-pixels = { $wide } × { $high } pixels. At most 50 million fit. Make it smaller.
