# Was der Server sagt, ehe die Werkstatt gefragt wird (api/edge).

api-edge-fault = Auf dem Server ging etwas schief. Sein Log sagt, was.
api-edge-busy = Zu viele fragen auf einmal. Bald noch einmal versuchen.
api-edge-too-often = Zu viele auf einmal. In 60 s noch einmal versuchen.
api-edge-unreadable = Das ist kein richtiges HTTP. Es ist nicht lesbar.
api-edge-too-long = Die Anfrage mit ihren Köpfen ist länger als { $most } Bytes.
api-edge-disk-full = Die Platte des Servers ist voll. Nichts wurde gespeichert. Platz schaffen, dann noch einmal senden.
