# Sinkside in a container: the web app, its WebAssembly core and a static binary are built in
# stages; what runs is the binary alone, as a user without rights, with its data in a volume.
#
#   docker build -t sinkside .
#   docker run -d --name sinkside -v sinkside:/data \
#     -p 127.0.0.1:8780:8780 -p 8743:8743 -p 8781:8781 \
#     -e SINKSIDE_ADVERTISE_ADDRESS=192.168.1.20 -e SINKSIDE_PUBLIC_NAME=studio-pc.local \
#     -e TZ=Europe/London sinkside
#   docker logs sinkside          # the first one-time links
#   docker exec sinkside /sinkside pair
#
# Multicast does not leave a container and it cannot see the machine's address on the network, so
# both are said: SINKSIDE_ADVERTISE_ADDRESS is the address by which phones reach the machine,
# SINKSIDE_PUBLIC_NAME a name that the network finds, such as the machine's own. Publish the plain
# port 8780 on 127.0.0.1 only; it is for the machine's own browser. Ports must be published under
# their own numbers, since the links name them.

FROM node:20-bookworm-slim AS npm
WORKDIR /src/pwa
COPY pwa/package.json pwa/package-lock.json ./
RUN npm ci --no-audit --no-fund

FROM golang:1.26-bookworm AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
COPY --from=npm /src/pwa/node_modules ./pwa/node_modules
# The web app's build installs its packages anew when the lockfile is newer than they are; here they were
# just installed from that same lockfile, whatever time the checkout gave it.
RUN touch pwa/node_modules/.package-lock.json && go run ./pwa/build
ARG VERSION=
# timetzdata: the image has no time zones of its own, and TZ decides what a day is.
RUN CGO_ENABLED=0 go build -trimpath -tags timetzdata -ldflags "-s -w -X main.version=${VERSION}" -o /out/sinkside ./server \
 && mkdir -p /out/data /out/tmp

FROM scratch
COPY --from=build /out/sinkside /sinkside
COPY --from=build --chown=10001:10001 /out/data /data
COPY --from=build --chown=10001:10001 /out/tmp /tmp
USER 10001:10001
ENV SINKSIDE_DATA=/data \
    SINKSIDE_LISTEN=0.0.0.0:8780 \
    SINKSIDE_NO_MDNS=true
VOLUME /data
EXPOSE 8780 8743 8781
STOPSIGNAL SIGTERM
HEALTHCHECK --interval=30s --timeout=5s --start-period=10s --retries=3 CMD ["/sinkside", "health"]
ENTRYPOINT ["/sinkside"]
CMD ["serve"]
