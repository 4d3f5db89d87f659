import { HomePage } from './overview/home-page.tsx'

export default function Home() {
  return <HomePage />
}
