# The maker's own pattern for batch numbers (bench/batch_number.py, frontend/bench/batch-number.js). token: a name in braces, “{"{"}mark{"}"}”.

batch-number-length = A pattern has from 1 to 60 characters.
batch-number-unknown = “{ $written }” is not known here. It could be { $could }.
batch-number-characters = Between the braces use letters, digits, spaces and . / # _ - only.
batch-number-needed = Add { $token }. Without it two devices with no connection could give one number twice.
batch-number-beside = Part { $token } from what stands beside it, with a - or a space.
batch-number-day = “{ $written }” is not a day such as 2026-11-25.
batch-number-mark = A device's mark is 1 to 4 capitals, A to Z.
batch-number-count = A device's count begins at 1.
