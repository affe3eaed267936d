FROM node:20-bookworm-slim

WORKDIR /app
ENV NEXT_TELEMETRY_DISABLED=1

# Packages first: they change less often than the sources.
COPY .npmrc package.json package-lock.json ./
COPY apps/api/package.json apps/api/
COPY apps/web/package.json apps/web/
COPY packages/config/package.json packages/config/
COPY packages/contract/package.json packages/contract/
COPY packages/database/package.json packages/database/
COPY packages/start/package.json packages/start/
COPY packages/trade/package.json packages/trade/
RUN npm ci --include=dev

COPY . .
RUN node packages/start/src/generate.js && node packages/start/src/build.js

USER node
ENV NODE_ENV=production HOST=0.0.0.0 PORT=3000
EXPOSE 3000
HEALTHCHECK --interval=30s --timeout=5s --start-period=30s \
  CMD node -e "fetch('http://127.0.0.1:' + process.env.PORT + '/health/ready').then((r) => process.exit(r.ok ? 0 : 1), () => process.exit(1))"
CMD ["node", "--import", "tsx", "apps/api/src/server.ts"]
