import { NotFoundScreen } from '#features/shell/not-found-screen.tsx'

export default function NotFound() {
  return <NotFoundScreen />
}
