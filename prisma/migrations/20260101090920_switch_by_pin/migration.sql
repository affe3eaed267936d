-- A shared tablet: who signed in on it in its present session, and the PIN by which each comes back.
CREATE TABLE "identity_pin" (
    "user_id" UUID NOT NULL,
    "hash" TEXT NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "identity_pin_pkey" PRIMARY KEY ("user_id")
);

CREATE TABLE "identity_device" (
    "id" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "session_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "identity_device_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "identity_device_person" (
    "device_id" UUID NOT NULL,
    "user_id" UUID NOT NULL,
    "signed_in_at" TIMESTAMPTZ(3) NOT NULL,
    "failed" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "identity_device_person_pkey" PRIMARY KEY ("device_id","user_id")
);

CREATE UNIQUE INDEX "identity_device_token_hash_key" ON "identity_device"("token_hash");
CREATE INDEX "identity_device_person_user_id_idx" ON "identity_device_person"("user_id");

ALTER TABLE "identity_pin" ADD CONSTRAINT "identity_pin_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "identity_user"("id") ON DELETE CASCADE ON UPDATE RESTRICT;
ALTER TABLE "identity_device_person" ADD CONSTRAINT "identity_device_person_device_id_fkey" FOREIGN KEY ("device_id") REFERENCES "identity_device"("id") ON DELETE CASCADE ON UPDATE RESTRICT;
ALTER TABLE "identity_device_person" ADD CONSTRAINT "identity_device_person_user_id_fkey" FOREIGN KEY ("user_id") REFERENCES "identity_user"("id") ON DELETE CASCADE ON UPDATE RESTRICT;

alter table identity_device add constraint identity_device_token_hash_length check (octet_length(token_hash) = 32);
grant select, insert, update, delete on identity_pin, identity_device, identity_device_person to curebook_identity;
