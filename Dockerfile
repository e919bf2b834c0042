# Bowlside with what a shared studio needs; compose.yaml says how it is started.
# A tag of one patch release (from memory); raise it with constraints.txt.
FROM python:3.12.12-slim-bookworm

COPY pyproject.toml constraints.txt README.md LICENSE /source/
COPY api /source/api
COPY bench /source/bench
COPY frontend /source/frontend
COPY demo /source/demo
RUN pip install --no-cache-dir --constraint /source/constraints.txt '/source[shared,plan]' && rm -r /source

RUN useradd --system bowlside && install --directory --owner bowlside /var/lib/bowlside
USER bowlside
WORKDIR /var/lib/bowlside
ENV BOWLSIDE_DATABASE=/var/lib/bowlside/bowlside.sqlite3
EXPOSE 8420
ENTRYPOINT ["bowlside"]
CMD ["serve"]
