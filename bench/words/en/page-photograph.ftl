# Taking a photograph (frontend/parts/photograph.js).

page-photograph-needs-https = Photographs need the studio's https address. Open this page there.
page-photograph-unread = This browser cannot read that file. Choose a picture.
page-photograph-too-large = The picture could not be made smaller. Take it again.
